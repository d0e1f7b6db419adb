/**
 * Light or dark by the reader's own choice, on pages that have no switch for it: the theme keeps it for the pages that
 * have one. Not a module, and nothing imported, so that it is done before anything is painted in the other scheme.
 */

(() => {
  const { src } = /** @type {HTMLScriptElement} */ (document.currentScript);
  const { pathname } = new URL("../../../", src);
  try {
    const { media, scheme } = JSON.parse(localStorage.getItem(`${pathname}.__palette`)).color;
    // The theme's third choice is to follow the device.
    if (media !== "(prefers-color-scheme)" && scheme) document.documentElement.dataset.mdColorScheme = scheme;
  } catch {
    // Nothing chosen, or nothing kept: the device chooses.
  }
})();
