"""What a label declares of a mixture: nutrients by US and EU rules, the list of ingredients, the serving."""
