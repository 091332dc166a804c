/** Hatching as plain lines, so that no renderer needs patterns. */
import type { Line, Point, Role } from './scene.ts';

/**
 * Lines rising to the right at 45°, `spacing` mm apart, inside a simple polygon. Exact for any simple polygon: each line
 * x + y = c is cut at its crossings with the edges and drawn between every odd and even one.
 */
export function hatchPolygon(points: Point[], spacing: number, role: Role = 'hatch'): Line[] {
  const sums = points.map((point) => point.x + point.y);
  const lines: Line[] = [];
  const first = Math.ceil(Math.min(...sums) / spacing) * spacing;
  const last = Math.max(...sums);
  for (let c = first; c <= last; c += spacing) {
    const crossings = crossingsAt(points, c);
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const from = crossings[i]!;
      const to = crossings[i + 1]!;
      lines.push({ kind: 'line', role, from: { x: from, y: c - from }, to: { x: to, y: c - to } });
    }
  }
  return lines;
}

/** The x of every crossing of the line x + y = `c` with the edges, sorted. An edge owns its lower end only. */
function crossingsAt(points: Point[], c: number): number[] {
  const crossings: number[] = [];
  for (let i = 0; i < points.length; i += 1) {
    const a = points[i]!;
    const b = points[(i + 1) % points.length]!;
    const atA = a.x + a.y - c;
    const atB = b.x + b.y - c;
    if (atA < 0 === atB < 0) continue;
    crossings.push(a.x + (b.x - a.x) * (atA / (atA - atB)));
  }
  return crossings.sort((p, q) => p - q);
}

export function hatchRect(x: number, y: number, width: number, height: number, spacing: number): Line[] {
  const corners = [
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ];
  return hatchPolygon(corners, spacing);
}
