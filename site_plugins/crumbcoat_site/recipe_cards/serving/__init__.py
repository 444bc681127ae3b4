"""What only a served site needs: its author looks at it while writing."""
