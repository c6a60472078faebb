"""One module for each area of the pages, each with its own router."""
