// True size: as many dots to a millimetre as the maker finds with a ruler, kept in this browser.
const slider = document.getElementById("scale");
const square = document.getElementById("square");
const cast = document.getElementById("cast");
const size = cast.viewBox.baseVal;
slider.value = localStorage.getItem("dots per mm") || slider.value;
function draw() {
  const dots = Number(slider.value);
  square.style.width = square.style.height = `${100 * dots}px`;
  cast.style.width = `${size.width * dots}px`;
  cast.style.height = `${size.height * dots}px`;
  slider.nextElementSibling.textContent = dots.toFixed(3);
  localStorage.setItem("dots per mm", String(dots));
}
slider.addEventListener("input", draw);
draw();
