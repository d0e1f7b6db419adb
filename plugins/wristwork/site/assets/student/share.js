/** On every page with an exercise: ways to pass it on. */

import { mountSharing } from "./sharing.js";

mountSharing();
