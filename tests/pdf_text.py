"""The words of a PDF, read by programs that had no hand in making it."""

import io

import pypdf
import pypdfium2


def words_of_pages(data: bytes) -> list[str]:
    """The text of each page as one sees it, one space between words; what lies outside the paper's edges is not read.

    By pdfium, which takes a fortieth of pypdf's time where pages share a large drawing.
    """
    opened = pypdfium2.PdfDocument(data)
    try:
        return [" ".join(page.get_textpage().get_text_bounded().split()) for page in opened]
    finally:
        opened.close()


def words_of(data: bytes) -> str:
    return " ".join(words_of_pages(data))


def letters_of_pages(data: bytes) -> list[str]:
    """The same by pypdf: in the order in which it was written, so that a letter stays with its accents."""
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(data)).pages]
