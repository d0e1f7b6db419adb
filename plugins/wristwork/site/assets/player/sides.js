/** On every page that names a hand: it says which one plays for this reader. */

import { startDiagrams } from "./diagram.js";

startDiagrams();
