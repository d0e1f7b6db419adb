// On a screen that is touched nothing can be pointed at: the first touch shows an exercise's bows, the second opens it.
if (matchMedia("(hover: none)").matches) {
  for (const map of document.querySelectorAll(".ww-needs-map")) {
    map.addEventListener("click", (event) => {
      /** @type {any} */
      const touched = event.target;
      const step = touched.closest(".ww-step");
      if (!step || step.classList.contains("ww-chosen")) return;
      event.preventDefault();
      map.querySelector(".ww-chosen")?.classList.remove("ww-chosen");
      step.classList.add("ww-chosen");
    });
  }
}
