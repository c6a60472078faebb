"""Paper: what is written as PDF, from the same pictures and words as the pages."""
