import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { hostname, tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { HistoryFault } from "../../src/history/history-fault.ts";
import { takeLock } from "../../src/history/history-lock.ts";
import { openToWrite } from "../../src/history/open-to-write.ts";

vi.setConfig({ testTimeout: 60_000 });

let folder = "";
let store = "";
let lock = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "lock-"));
  store = join(folder, "history.sqlite");
  lock = `${store}.lock`;
});
afterEach(() => rmSync(folder, { recursive: true }));

const since = "2026-01-15T02:00:00.000Z";
const ownedBy = (owner: object): void => writeFileSync(lock, JSON.stringify(owner));
const faultOf = (): HistoryFault | null => {
  try {
    takeLock(store).release();
  } catch (error) {
    if (error instanceof HistoryFault) return error;
    throw error;
  }
  return null;
};

/** A process of its own that takes the lock, says "held" or the code of the refusal, and then does `after`. */
const script = (after: string): string[] => [
  "--input-type=module",
  "-e",
  `import { takeLock } from ${JSON.stringify(resolve("src/history/history-lock.ts"))};
  try { takeLock(${JSON.stringify(store)}); process.stdout.write("held\\n"); }
  catch (error) { process.stdout.write(error.reason.code + "\\n"); }
  ${after}`,
];
/** A process that was killed while it held the lock; its number. */
const killedHolder = (): number => {
  const { pid, signal, stdout } = spawnSync(
    process.execPath,
    script('process.kill(process.pid, "SIGKILL"); await new Promise(() => setInterval(() => {}));'),
    { encoding: "utf8" },
  );
  expect([stdout, signal]).toEqual(["held\n", "SIGKILL"]);
  return pid;
};

describe("takeLock", () => {
  test("names the owner while it is held, and leaves nothing when it is released", () => {
    const held = takeLock(store);
    expect(JSON.parse(readFileSync(lock, "utf8"))).toMatchObject({
      pid: process.pid,
      host: hostname(),
    });
    expect(faultOf()?.reason.code).toBe("history-in-use");
    expect(faultOf()?.message).toContain(`process ${process.pid} on ${hostname()} since 20`);
    held.release();
    expect(readdirSync(folder)).toEqual([]);
    expect(faultOf()).toBeNull();
  });

  test("the lock of a process that was killed is taken over with a note", () => {
    const pid = killedHolder();
    const { notes, release } = takeLock(store);
    expect(notes.map(({ code, data }) => [code, data["pid"]])).toEqual([
      ["history-lock-left-behind", pid],
    ]);
    expect(JSON.parse(readFileSync(lock, "utf8"))).toMatchObject({ pid: process.pid });
    release();
    expect(readdirSync(folder)).toEqual([]);
  });

  test("an earlier process with this process's number has left its lock behind", () => {
    ownedBy({ pid: process.pid, host: hostname(), since: "2001-01-01T00:00:00.000Z" });
    const { notes, release } = takeLock(store);
    expect(notes.map(({ code }) => code)).toEqual(["history-lock-left-behind"]);
    release();
  });

  test.each([
    ["of another host", () => ({ pid: 1, host: `not-${hostname()}`, since }), "since 2026-01-15"],
    ["of a living process", () => ({ pid: process.ppid, host: hostname(), since }), "process"],
    ["that says nothing", () => ({}), "(unknown)"],
  ])("a lock %s stays", (_, owner, words) => {
    ownedBy(owner());
    const before = readFileSync(lock);
    const fault = faultOf();
    expect(fault?.reason.code).toBe("history-in-use");
    expect(fault?.message).toContain(words);
    expect(fault?.message).toContain(`delete ${lock}`);
    expect(readFileSync(lock).equals(before)).toBe(true);
    expect(readdirSync(folder)).toEqual(["history.sqlite.lock"]);
  });

  test("a lock that is being taken over by another process is left to it", () => {
    killedHolder();
    writeFileSync(`${lock}.takeover`, JSON.stringify({ pid: 1, host: "other", since }));
    expect(faultOf()?.message).toContain(`process 1 on other since ${since}`);
    expect(existsSync(`${lock}.takeover`)).toBe(true);
  });

  test("a lock that someone deleted and another run took is not released for it", () => {
    const first = takeLock(store);
    ownedBy({ pid: 1, host: "other", since });
    first.release();
    expect(existsSync(lock)).toBe(true);
  });

  test("of many processes that find a lock left behind, one gets it", async () => {
    killedHolder();
    const children = Array.from({ length: 6 }, () =>
      spawn(process.execPath, script("process.stdin.resume();")),
    );
    const answers = await Promise.all(children.map(answerOf));
    for (const child of children) child.stdin?.end();
    expect(answers.toSorted()).toEqual(["held", ...Array(5).fill("history-in-use")]);
  });
});

const answerOf = (child: ChildProcess): Promise<string> =>
  new Promise((done) => {
    child.stdout?.once("data", (line: Buffer) => done(line.toString().trim()));
  });

test("a store that is in use is not even made", () => {
  const held = takeLock(store);
  expect(() => openToWrite(store)).toThrow(HistoryFault);
  expect(existsSync(store)).toBe(false);
  held.release();
  const { history, notes, close } = openToWrite(store);
  expect([notes, history.latestNight(), existsSync(lock)]).toEqual([[], 0, true]);
  close();
  expect(readdirSync(folder)).toEqual(["history.sqlite"]);
});
