"""The command `crumbcoat`: begins a site or a recipe, checks files, shows figures, serves and builds."""
