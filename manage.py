#!/usr/bin/env python3
"""The workshop's one command: python3 manage.py demo, start, test, doctor, jobsheet."""
# This file is read by whatever Python there is, so it keeps to what every Python can read.

import sys


def main():
    if sys.version_info < (3, 11):
        sys.exit(
            "Chalk & Calendar needs Python 3.11 or newer; this is Python %d.%d (%s). "
            "Install a newer one and run it as, for instance, python3.11 manage.py."
            % (sys.version_info[0], sys.version_info[1], sys.executable)
        )
    from workshop import bootstrap

    bootstrap.enter(sys.argv)
    from django.core.management import execute_from_command_line

    execute_from_command_line(sys.argv)


if __name__ == "__main__":
    main()
