"""Pattern → MusicXML 4.0, from the same score that the diagram is drawn from."""

from wristwork.exchange.score.document import score_bytes

__all__ = ["score_bytes"]
