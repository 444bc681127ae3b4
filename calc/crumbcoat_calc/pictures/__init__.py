"""Pictures of results: plain data in, SVG text out, the same in the build and in the browser."""
