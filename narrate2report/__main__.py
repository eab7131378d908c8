"""`python -m narrate2report` is the same as the installed command."""

import sys

from narrate2report.cli import main

sys.exit(main())
