/** On every page with an exercise: its players. */

import { startPlayers } from "./players.js";

startPlayers();
