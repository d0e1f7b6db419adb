/**
 * The outlines of forearm, hand and stick, five pixels to the centimetre, as the drawings of the safe-practice pages have
 * them (`site/safety/drawings/hand.py`): each in its own coordinates, ahead to the right.
 */

/** From the elbow at 0 0 to the wrist. */
export const FOREARM =
  "M1.3 -21L140.8 -12.5A12.5 12.5 0 0 1 140.8 12.5L1.3 21A21 21 0 1 1 1.3 -21Z";
/** The wrist at 0 0, the knuckles ahead of it. */
export const PALM =
  "M-5 -12.4 C8 -15 26 -19.5 37 -18 C46 -16.8 55 -9 60.5 -1 C65 5.5 64.5 13 59 16.5 C54 19.5 48.5 18.5 44.5 20.5 " +
  "C37 24.5 22 23.5 13 19 C7 16.5 2 13 -5 12.4 Z";
/** On the palm. */
export const THUMB =
  "M1 4 C8 -2.5 18 -4 27 -2.4 C36 -1 44 0 51 2 C57.5 4 58 11 52 12.4 C45 14 37 13 31 13.8 C22 15 13 17 6 12.5";
/** Lines on the palm. */
export const FINGERS =
  "M43 -3.4 C50 -4.5 55 -2.5 57.5 1M59 16.5 C55 21.5 46.5 22 45 18.2M45.5 21 C41 25.5 33 25 32.2 20.8M32.5 23.8 " +
  "C28 26.4 21 25 20.2 21";
/** Finer lines on it. */
export const CREASES =
  "M49 4.4 C52.4 4.6 54.6 6.2 54.6 8.2M36.5 -17.5 C40.5 -14.5 41.5 -11 40 -8";
/** The whole stick, held at 0 0. */
export const STICK =
  "M-66 -3.9L52.8 -3.6A3.6 3.6 0 0 1 52.8 3.6L-66 3.9A3.9 3.9 0 1 1 -66 -3.9ZM52.9 -3.6L125 -1.9A1.9 1.9 0 0 1 " +
  "125 1.9L52.9 3.6A3.6 3.6 0 1 1 52.9 -3.6ZM124.7 -2.2L131.5 -3.2A3.2 3.2 0 1 1 131.5 3.2L124.7 2.2A2.2 2.2 0 0 " +
  "1 124.7 -2.2Z";
/** The part of it that lies over the palm. */
export const STICK_AHEAD =
  "M-12 -3.9L52.8 -3.6A3.6 3.6 0 0 1 52.8 3.6L-12 3.9A3.9 3.9 0 1 1 -12 -3.9ZM52.9 -3.6L125 -1.9A1.9 1.9 0 0 1 " +
  "125 1.9L52.9 3.6A3.6 3.6 0 1 1 52.9 -3.6ZM124.7 -2.2L131.5 -3.2A3.2 3.2 0 1 1 131.5 3.2L124.7 2.2A2.2 2.2 0 0 " +
  "1 124.7 -2.2Z";
