"""Statistics of trials, by scipy: an extra of the package, used in the terminal and never by a build or a browser."""
