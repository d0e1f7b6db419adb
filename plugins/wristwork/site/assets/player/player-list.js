/** The players of the page, by their figures. It knows no player itself, so whatever a player is made of may ask it. */

/** @type {Map<HTMLElement, import("./player-figure.js").Player>} */
export const players = new Map();

/** How figures get players; set by whoever starts the players of a page. @type {{mount: ((root: ParentNode) => any[])|null}} */
export const makers = { mount: null };

/** The player of a figure, if it has one. */
export const playerOf = (figure) => players.get(figure) ?? null;

/** All players, in the order of the page. */
export const playersOnPage = () => [...document.querySelectorAll(".ww-exercise")].map(playerOf).filter(Boolean);
