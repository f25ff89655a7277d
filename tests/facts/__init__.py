"""Moments, and whatever else of the nouns stands without a judgement."""
