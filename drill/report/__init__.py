"""Plans, questions and progress as text, for a terminal or a file. Nothing is decided here, only said."""
