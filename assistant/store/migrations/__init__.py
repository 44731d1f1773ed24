"""The steps by which the tables came to their present form; run by `Store.upgrade`."""
