"""What the options of all our plug-ins have in common: a name that does not exist is an error, with its place."""
