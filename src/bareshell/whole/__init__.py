"""The car as one: what one subject asks of another.

The five subjects do not know each other; here they are joined. A build becomes the problem
the plan solves, what a person says becomes changes, an entry becomes a sentence.
"""
