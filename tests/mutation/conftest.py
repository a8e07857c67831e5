"""Lets the tests beside it import the cases as written and the ways to break a rulebook."""

import importlib.util
import sys
from pathlib import Path

_TESTS = Path(__file__).parent.parent
_MODULES = {
    "written_cases": _TESTS / "cases" / "written_cases.py",
    "case_figures": _TESTS / "cases" / "case_figures.py",
    "mutants": _TESTS / "mutation" / "mutants.py",
    "broken_limits": _TESTS / "mutation" / "broken_limits.py",
    "question_keys": _TESTS / "mutation" / "question_keys.py",
}
for _name, _path in _MODULES.items():
    if _name not in sys.modules:
        _spec = importlib.util.spec_from_file_location(_name, _path)
        assert _spec is not None
        assert _spec.loader is not None
        sys.modules[_name] = importlib.util.module_from_spec(_spec)
        _spec.loader.exec_module(sys.modules[_name])
