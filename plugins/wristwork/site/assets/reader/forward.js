/** A moved exercise: goes on to its new place, and takes the tempo in the address along. */

const target = new URL(document.querySelector(".ww-forward").getAttribute("href"), location.href);
target.search = location.search;
target.hash = location.hash;
location.replace(target);
