"""Lets the tests beside it import the cases as written, which are no package of their own."""

import importlib.util
import sys
from pathlib import Path

for _name in ("written_cases", "case_figures"):
    if _name not in sys.modules:
        _spec = importlib.util.spec_from_file_location(_name, Path(__file__).parent / f"{_name}.py")
        assert _spec is not None
        assert _spec.loader is not None
        sys.modules[_name] = importlib.util.module_from_spec(_spec)
        _spec.loader.exec_module(sys.modules[_name])
