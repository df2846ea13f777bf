import { createReadStream, createWriteStream, existsSync, readFileSync } from "node:fs";
import { mkdir, mkdtemp, rename, rm, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { homedir } from "node:os";
import { basename, dirname, join } from "node:path";
import { pipeline } from "node:stream/promises";
import { brotliDecompressSync, createBrotliDecompress } from "node:zlib";

const require = createRequire(import.meta.url);
const chunkBytes = 1 << 21;
const tarBlock = 512;

/** Folder of the package that carries a browser for 64-bit Linux; null where it is not installed. */
function packageFolder(): string | null {
  try {
    return dirname(dirname(require.resolve("@sparticuz/chromium")));
  } catch {
    return null;
  }
}

const cacheFolder = (): string => process.env["XDG_CACHE_HOME"] ?? join(homedir(), ".cache");

const octal = (block: Buffer, start: number, end: number): number =>
  Number.parseInt(block.toString("latin1", start, end), 8);

/** The plain files of a tar archive. Source: POSIX.1-1988, ustar interchange format. */
function tarFiles(archive: Buffer): { name: string; content: Buffer }[] {
  const files: { name: string; content: Buffer }[] = [];
  for (let at = 0; at < archive.length && archive[at] !== 0;) {
    const header = archive.subarray(at, at + tarBlock);
    const [name = ""] = header.toString("latin1", 0, 100).split("\0");
    const size = octal(header, 124, 136);
    const content = archive.subarray(at + tarBlock, at + tarBlock + size);
    if (header.toString("latin1", 156, 157) === "0") files.push({ name: basename(name), content });
    at += tarBlock + Math.ceil(size / tarBlock) * tarBlock;
  }
  return files;
}

async function unpack(source: string, target: string): Promise<void> {
  await pipeline(
    createReadStream(join(source, "bin", "chromium.br"), { highWaterMark: chunkBytes }),
    createBrotliDecompress({ chunkSize: chunkBytes }),
    createWriteStream(join(target, "chromium"), { mode: 0o700 }),
  );
  const archive = brotliDecompressSync(readFileSync(join(source, "bin", "al2023.tar.br")));
  await mkdir(join(target, "lib"));
  for (const { name, content } of tarFiles(archive))
    await writeFile(join(target, "lib", name), content, { mode: 0o700 });
}

/** A browser that ships inside an npm package. */
export interface BundledBrowser {
  executable: string;
  /** Shared libraries for machines that have none of their own. */
  libraries: string;
}

/**
 * The browser of the optional package, unpacked once into the user's cache folder; null where the package or the
 * platform is another. It is unpacked under another name and then renamed, so a broken-off run leaves no half browser.
 */
export async function bundledBrowser(): Promise<BundledBrowser | null> {
  const source = packageFolder();
  if (source === null || process.platform !== "linux" || process.arch !== "x64") return null;
  const { version } = JSON.parse(readFileSync(join(source, "package.json"), "utf8")) as {
    version: string;
  };
  const parent = join(cacheFolder(), "aortic-packet");
  const folder = join(parent, `chromium-${version}`);
  if (!existsSync(folder)) {
    await mkdir(parent, { recursive: true });
    const unfinished = await mkdtemp(`${folder}-unfinished-`);
    await unpack(source, unfinished);
    try {
      await rename(unfinished, folder);
    } catch (error) {
      await rm(unfinished, { recursive: true });
      if (!existsSync(folder)) throw error;
    }
  }
  return { executable: join(folder, "chromium"), libraries: join(folder, "lib") };
}
