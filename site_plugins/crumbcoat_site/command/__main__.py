"""`python -m crumbcoat_site.command` is the command `crumbcoat`."""

from crumbcoat_site.command.main import crumbcoat

if __name__ == "__main__":
    crumbcoat(prog_name="crumbcoat")
