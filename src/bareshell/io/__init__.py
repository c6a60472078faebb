"""Files that come from and go to the outside: photographs, sheets, build files, archives.

Everything that arrives here may be cut short, foreign or made to harm: each reader says in a
sentence what is wrong and lets nothing through by halves.
"""
