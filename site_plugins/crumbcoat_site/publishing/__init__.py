"""MkDocs plug-in: what a host sends with each file of a built site, as files for hosts, as a server, and as a check."""
