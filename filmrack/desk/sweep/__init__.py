"""The screen Sweep: the dryer gone through rod by rod.

- How it stands, as the file has it: `course` reads the sweep, `turn` is one rod of it.
- Where this desk is in it: `place`.
- What keys and lines do: `sweeper` takes them, `lines` tells what a line is, `names` whose strip a
  name means, `numbers` whether a bare number is a count or a clip. `at_rod` does what is told of a
  whole rod, by `counts` and `boxing`, `strips` what is told of one strip, by `scans`, `untold` and
  `missing`.
  Both ask by `questions`, and `asked` holds an answer to the rod that was asked about. `end`,
  `slips` and `taking_back` do the rest.
- What is shown: `view` draws `rod_list` at the left and a `page` at the right, which `rod_page` and
  `end_page` fill, with `figures` to be read from a step away.
- Words that several of them say: `rod_words`, `ways`, `remarks`.
"""
