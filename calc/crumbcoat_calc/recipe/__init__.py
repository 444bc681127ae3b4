"""A recipe as calc sees it: `model` what it is, `reading` how it is read, `batch` what a batch of it is made of."""
