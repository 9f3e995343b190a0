// The one shape in which anything that goes wrong reaches the screens.

export type Place = { path: string; message: string };
export type Trouble = { code: string; message: string; places: Place[] };

/** Turns whatever was thrown into a `Trouble`; something unforeseen still gives a readable sentence. */
export function troubleOf(thrown: unknown): Trouble {
  if (typeof thrown === "object" && thrown !== null && "code" in thrown && "message" in thrown) {
    const { code, message } = thrown;
    const places = "places" in thrown && Array.isArray(thrown.places) ? (thrown.places as Place[]) : [];
    return { code: String(code), message: String(message), places };
  }
  const message = thrown instanceof Error ? thrown.message : String(thrown);
  return { code: "failed", message, places: [] };
}
