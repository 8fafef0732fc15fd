"""The faces of Strandproof: use cases (`workflow`) and the command line (`cli`).

`workflow` may import every part; `cli` only `workflow`, `records` and `errors`.
"""
