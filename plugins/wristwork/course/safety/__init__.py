"""Hands and ears: facts with sources, breaks, exposure to sound, warm-up, the safe-practice pages' rules."""
