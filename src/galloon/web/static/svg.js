// An SVG element with its attributes.
export function svg(tag, keys) {
  const made = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [key, value] of Object.entries(keys)) made.setAttribute(key, value);
  return made;
}
