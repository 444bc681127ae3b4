"""Runs in Pyodide before the snapshot: forgets the files that the browser will not have, then collects garbage.

`modules` is the JSON list of the modules that the snapshot holds.
"""

import gc
import json
import linecache
import sys
import zipimport

linecache.clearcache()
sys.path_importer_cache.clear()
vars(zipimport)["_zip_directory_cache"].clear()
modules = json.dumps(sorted(sys.modules))
sys.modules["__main__"].__dict__.pop("__warningregistry__", None)
gc.collect()
