"""The check of a site that is published already: what its host really sends."""
