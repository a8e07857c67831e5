"""One kind of question a module: an item to a question in that kind."""
