"""The drum kit, made by computation: what is struck, how it rings, what it is held to."""

from wristwork.sound.kit.kit import Kit
from wristwork.sound.kit.voices import Sound, Voice, voice_of

__all__ = ["Kit", "Sound", "Voice", "voice_of"]
