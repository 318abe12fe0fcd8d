// The Draft page: touching a line, or reaching it with Tab, says its length and marks its step.
// Without this file the page is complete; every line still has its name and length as a title.
(() => {
  const said = document.querySelector("[data-line-said]");
  if (!said) return;
  const svgSpace = "http://www.w3.org/2000/svg";
  let kept = null;

  // A step names its lines as one word each ("cup-seam"); a dart parts an edge into "waist 1" and "waist 2".
  const markOf = (edge) => edge.replace(/ \d+$/, "").replaceAll(" ", "-");
  const outsideOf = (piece) => piece.replace(/ lining$/, "");

  const stepsOf = (line) =>
    [...document.querySelectorAll("[data-step]")].filter(
      (step) =>
        step.dataset.piece === outsideOf(line.dataset.piece) &&
        step.dataset.marks.split("|").includes(markOf(line.dataset.edge)),
    );

  const lift = (line) => {
    document.querySelectorAll(".is-touched").forEach((mark) => mark.classList.remove("is-touched"));
    document.querySelectorAll(".touched-length").forEach((mark) => mark.remove());
    kept = line;
  };

  const writeLength = (line) => {
    const drawing = line.ownerSVGElement;
    const middle = line.getPointAtLength(line.getTotalLength() * 0.35);
    const box = drawing.viewBox.baseVal;
    const words = document.createElementNS(svgSpace, "text");
    const leftHalf = middle.x < box.x + box.width / 2;
    words.setAttribute("class", "touched-length");
    words.setAttribute("x", middle.x + (leftHalf ? 12 : -12));
    words.setAttribute("y", middle.y);
    words.setAttribute("text-anchor", leftHalf ? "start" : "end");
    words.setAttribute("font-size", "25.4");
    words.textContent = line.dataset.length;
    drawing.append(words);
  };

  const touch = (line) => {
    if (line === kept) return;
    lift(line);
    line.classList.add("is-touched");
    writeLength(line);
    const steps = stepsOf(line);
    steps.forEach((step) => step.classList.add("is-touched"));
    const name = document.createElement("b");
    const told = `${line.dataset.edge} of the ${line.dataset.piece}: ${line.dataset.length} ${said.dataset.lineSaid}.`;
    name.textContent = told[0].toUpperCase() + told.slice(1);
    const story = steps.map((step) => `Step ${step.dataset.step}: ${step.querySelector("[data-text]").textContent.trim()}`).join(" ");
    said.replaceChildren(name, ` ${story}`);
  };

  for (const event of ["focusin", "pointerover", "click"]) {
    document.addEventListener(event, (happened) => {
      const line = happened.target.closest?.(".touch");
      if (line) touch(line);
    });
  }
})();
