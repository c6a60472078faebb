"""The pages: parse what a browser sends, make one call, show the result as HTML or JSON.

`application.create_app` builds the whole; `serve.serve` runs it. Every page works without
JavaScript and has a ``.json`` twin made from the same frozen context. Nothing here computes,
and nothing here opens a store.
"""
