"""Pictures: upright, without what a camera writes into them, and in the sizes that pages ask for."""
