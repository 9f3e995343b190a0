import { describe, expect, it } from "vitest";
import { Burst, HAND_MS, keyOf, looksLikeLabel, type Press, SEPARATOR } from "./burst";

const LABEL = "0109520000000017" + "17341105" + "10T228401";

function typed(text: string, every: number): { burst: Burst; at: number } {
  const burst = new Burst();
  let at = 1000;
  for (const letter of text) burst.sent(letter, (at += every));
  return { burst, at };
}

describe("a burst of keys", () => {
  it("is a scan when it is faster than hands", () => {
    const { burst, at } = typed(LABEL, 8);
    expect(burst.end(at + 8)).toBe(LABEL);
    expect(burst.end(at + 16), "only once").toBeUndefined();
  });

  it("is still one at the slowest speed of a scanner, and none above it", () => {
    const slow = typed(LABEL, HAND_MS);
    expect(slow.burst.end(slow.at + 10)).toBe(LABEL);
    const hand = typed(LABEL, HAND_MS + 1);
    expect(hand.burst.end(hand.at + 10)).toBeUndefined();
  });

  it("begins anew after a pause, so that what a hand typed before is no part of it", () => {
    const { burst, at } = typed("abc", 90);
    let now = at + 400;
    const sent = [...LABEL].map((letter) => burst.sent(letter, (now += 5)));
    expect(sent[0]).toEqual({ count: 1, fast: false });
    expect(sent.at(-1)).toEqual({ count: LABEL.length, fast: true });
    expect(burst.end(now)).toBe(LABEL);
  });

  it("stays whole when a busy computer hands on some of its keys late", () => {
    const burst = new Burst();
    let now = 0;
    for (const [place, letter] of [...LABEL].entries()) burst.sent(letter, (now += place % 5 === 1 ? 120 : 8));
    expect(burst.end(now)).toBe(LABEL);
  });

  it("goes on over the shift key", () => {
    const burst = new Burst();
    burst.sent("+", 0);
    burst.held(30);
    expect(burst.sent("H", 60), "each step is fast").toEqual({ count: 2, fast: true });
  });

  it("is none when it is forgotten, too short or too long ago", () => {
    const broken = typed(LABEL, 5);
    broken.burst.forget();
    expect(broken.burst.end(broken.at)).toBeUndefined();
    const short = typed("10AB", 5);
    expect(short.burst.end(short.at)).toBeUndefined();
    const old = typed(LABEL, 5);
    expect(old.burst.end(old.at + 5000)).toBeUndefined();
  });
});

describe("keys", () => {
  const none: Press = { key: "", ctrlKey: false, metaKey: false, altKey: false, repeat: false };
  function check(press: Partial<Press>, expected: ReturnType<typeof keyOf>) {
    expect(keyOf({ ...none, ...press }), JSON.stringify(press)).toEqual(expected);
  }

  it("are letters, separators or the end", () => {
    check({ key: "A" }, { is: "sent", text: "A" });
    check({ key: "]", ctrlKey: true }, { is: "sent", text: SEPARATOR });
    check({ key: SEPARATOR }, { is: "sent", text: SEPARATOR });
    check({ key: SEPARATOR, ctrlKey: true }, { is: "sent", text: SEPARATOR });
    check({ key: "]", ctrlKey: true, altKey: true }, { is: "sent", text: "]" });
    check({ key: "Enter" }, { is: "end" });
    check({ key: "Tab" }, { is: "end" });
    check({ key: "Shift" }, { is: "held" });
  });

  it("of a hand break a scan off", () => {
    check({ key: "a", repeat: true }, { is: "other" });
    check({ key: "c", ctrlKey: true }, { is: "other" });
    check({ key: "ArrowDown" }, { is: "other" });
  });
});

describe("the look of a label", () => {
  function check(text: string, expected: boolean) {
    expect(looksLikeLabel(text), JSON.stringify(text)).toBe(expected);
  }

  it("is known", () => {
    check(LABEL, true);
    check(`]d2${LABEL}`, true);
    check(`]C1\u001d${LABEL}`, true);
    check("(01)09520000000017(10)T228401", true);
    check("10T228401", true);
    check("1734110510T228401", true);
    check("+H123ABC01234567890D", true);
    check("+$$3250110LOT77K", true);
    check("=W0000123456780", true);
  });

  it("is not that of words, dates and numbers", () => {
    for (const text of ["", "10T2284", "Quennell", "2026-03-04", "20260304", "10 March 2027", "11.03.2027", "0109520"]) {
      check(text, false);
    }
  });
});
