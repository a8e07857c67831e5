"""Items as written, to questions whose key the planner decides."""
