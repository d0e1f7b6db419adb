/** On every page: the course at hand without a signal. */

import { keepsAnything, startKeeping } from "./keeping.js";

if (keepsAnything()) startKeeping();
