"""The reference pages of the demo site, written from the code that they describe: `make reference`."""
