"""One function per published equation: SI floats (or numpy arrays where said) in, SI out; no plan, no files.

Every public function in the subject modules keeps the docstring contract that `formulas.contract` reads: it is how
`pinfold formula` calls and explains it without code of its own.
"""
