/** On every page with an exercise: the student's own marks. */

import { startLog } from "./log-marks.js";

startLog();
