import { patientKey } from "../cases/identity.ts";
import type { PatientFile } from "../cases/patient-files.ts";
import type { FileAside } from "../cases/persons.ts";
import type { History } from "../history/history.ts";

/**
 * The files that someone took out of the folder to end a contradiction: stored on an earlier night, never used, not in
 * tonight's folder, while another file of the contradiction that is as old or older is there. Where the folder is
 * emptied every night none of them is there, and the contradiction stays until the site decides.
 */
export function withdrawnFiles(
  aside: FileAside[],
  inFolder: ReadonlySet<string>,
  { history, issuer }: { history: History; issuer: string | null },
): PatientFile[] {
  const waiting = aside.filter(({ why }) => why !== "decided").map(({ file }) => file);
  const byPatient = Map.groupBy(waiting, ({ stated }) =>
    patientKey(stated.id, stated.issuer ?? issuer),
  );
  return [...byPatient.values()].flatMap((files) => {
    const aged = files.map((file) => {
      const sha256 = file.stated.source.sha256 ?? "";
      return { file, stored: history.stored(sha256), isThere: inFolder.has(sha256) };
    });
    const there = aged.flatMap(({ stored, isThere }) => (isThere && stored ? stored.night : []));
    const oldest = Math.min(...there);
    return aged
      .filter(({ stored, isThere }) => !isThere && stored && !stored.isSettled)
      .filter(({ stored }) => oldest <= (stored?.night ?? 0))
      .map(({ file }) => file);
  });
}
