"""The command line: parse, one call into ``app``, show. The same words as the pages.

``bareshell --help`` must answer at once in a cold garage, so commands are loaded when called.
"""
