// Shapes of the drawing board: track, its names and signs, the corners of the picture; y downward.
const svgName = 'http://www.w3.org/2000/svg';

export function lineOf(line, isChosen) {
  const d = pathOf(line.points);
  const group = make('g', { class: `line ${line.kind}${isChosen ? ' chosen' : ''}`, 'data-of': line.piece });
  group.append(...['touch', 'rails', 'between'].map(kind => make('path', { class: kind, d })));
  return group;
}

export function nameOf(line) {
  const middle = line.points[Math.floor((line.points.length - 1) / 2)];
  const next = line.points[Math.floor((line.points.length - 1) / 2) + 1] ?? middle;
  const words = make('text', { y: -10 });
  words.textContent = line.piece;
  return sign({ x: (middle.x + next.x) / 2, y: (middle.y + next.y) / 2 }, `name ${line.kind}`, [words]);
}

export function sign(at, kind, shapes) {
  const group = make('g', { class: kind });
  group.at = at;
  group.append(...shapes);
  return group;
}

export function cornersOf(picture) {
  if (!picture) return [];
  const angle = picture.turn * Math.PI / 180;
  return [[0, 0], [1, 0], [0, 1], [1, 1]].map(([across, up]) => {
    const [x, y] = [across * picture.width, up * picture.height];
    return { x: picture.x + x * Math.cos(angle) - y * Math.sin(angle), y: -(picture.y + x * Math.sin(angle) + y * Math.cos(angle)) };
  });
}

export function make(name, attributes) {
  const element = document.createElementNS(svgName, name);
  set(element, attributes);
  return element;
}

export function set(element, attributes) {
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
}

export const pathOf = points => points.map((at, i) => `${i === 0 ? 'M' : 'L'}${at.x} ${at.y}`).join('');
