"""What is kept on disk: the attempt log, and the compiled book that every front opens."""
