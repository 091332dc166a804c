/** A scene that is narrow is set in the middle of a wider one: a page draws every scene as wide as itself, letters and all. */
import { group, type Scene } from './scene.ts';

/** The scene at least `least` mm wide. */
export function widenScene(scene: Scene, least: number): Scene {
  if (scene.width >= least) return scene;
  return { ...scene, width: least, shapes: [group({ x: (least - scene.width) / 2, y: 0 }, scene.shapes)] };
}
