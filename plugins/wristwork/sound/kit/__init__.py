"""The drum kit, made by computation: what is struck, how it rings, what it is held to."""

from wristwork.sound.kit.kit import Kit
from wristwork.sound.kit.voices import Clip, KitVoice, Sound, voice_of

__all__ = ["Clip", "Kit", "KitVoice", "Sound", "voice_of"]
