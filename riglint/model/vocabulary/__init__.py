"""Words, kinds of part and field types of the documents, each with its unit and its bounds."""
