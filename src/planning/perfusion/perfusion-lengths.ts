import type { Centreline, Exam, PatientCase } from "../../cases/patient-case.ts";
import { formatLength } from "../../quantities/format-length.ts";

/** A length along the centreline, mm, or what would have to be measured for it. Its error is not known. */
export type AorticLength = { mm: number; how: string; used: string[] } | { missing: string };

/** Zones whose beginning a length can be taken from. */
export type BeginZone = "0" | "1" | "2" | "3" | "4" | "5";

/** The mark at which each zone of the usual arch begins, and how far beyond it. Zone 3 is 2 cm long by definition. */
const begins: Record<BeginZone, { placeId: string; isBranch: boolean; beyondMm: number }> = {
  "0": { placeId: "sinotubular-junction", isBranch: false, beyondMm: 0 },
  "1": { placeId: "innominate-artery", isBranch: true, beyondMm: 0 },
  "2": { placeId: "left-common-carotid-artery", isBranch: true, beyondMm: 0 },
  "3": { placeId: "left-subclavian-artery", isBranch: true, beyondMm: 0 },
  "4": { placeId: "left-subclavian-artery", isBranch: true, beyondMm: 20 },
  "5": { placeId: "mid-descending", isBranch: false, beyondMm: 0 },
};

/**
 * From the beginning of a zone to the coeliac artery by the latest exam up to `asOf` (YYYY-MM-DD) that has it: between
 * edges marked on the centreline, which are of the usual arch, else the sum of the lengths measured in the zones.
 */
export function lengthToCoeliac(
  patientCase: PatientCase,
  asOf: string,
  zone: BeginZone,
  isUsualArch: boolean,
): AorticLength {
  for (const exam of patientCase.exams.toReversed()) {
    if (exam.imagingDate > asOf) continue;
    const length =
      (isUsualArch ? betweenMarks(patientCase, exam, zone) : null) ??
      sumOfZones(patientCase, exam, zone) ??
      (zone === "3" ? ofDescending(patientCase, exam) : null);
    if (length !== null) return length;
  }
  return {
    missing: `length from the beginning of zone ${zone} to the coeliac artery, along the centreline`,
  };
}

function betweenMarks(
  { centrelines }: PatientCase,
  exam: Exam,
  zone: BeginZone,
): AorticLength | null {
  const aorta = centrelines.find(({ exam: key, vessel }) => key === exam.key && vessel === "aorta");
  if (!aorta) return null;
  const { placeId, isBranch, beyondMm } = begins[zone];
  const start = markAt(aorta, placeId, isBranch ? "distal edge" : null);
  const end =
    markAt(aorta, "coeliac-artery", "proximal edge") ?? markAt(aorta, "at-coeliac-origin", null);
  if (start === null || end === null) return null;
  const mm = end.mm - start.mm - beyondMm;
  return mm <= 0
    ? null
    : {
        mm,
        how: `${formatLength(mm)} between marks on the centreline, ${exam.imagingDate}`,
        used: [start.key, end.key],
      };
}

function markAt(
  { stations }: Centreline,
  placeId: string,
  edge: "distal edge" | "proximal edge" | null,
): { mm: number; key: string } | null {
  const station = stations.find(({ mark }) => mark?.place.id === placeId && mark.edge === edge);
  return station ? { mm: station.distanceMm, key: station.key } : null;
}

const isLengthwise = (path: string): boolean => path === "centreline" || path === "unstated";

function lengthAt({ measurements }: PatientCase, exam: Exam, placeId: string) {
  const own = measurements.filter(
    (one) =>
      one.exam === exam.key &&
      one.place.id === placeId &&
      one.quantity === "length" &&
      isLengthwise(one.path),
  );
  return own.find(({ path }) => path === "centreline") ?? own[0] ?? null;
}

function sumOfZones(patientCase: PatientCase, exam: Exam, zone: BeginZone): AorticLength | null {
  const lengths = zoneOrder
    .slice(zoneOrder.indexOf(zone))
    .map((id) => lengthAt(patientCase, exam, `zone-${id}`));
  const known = lengths.flatMap((one) => one ?? []);
  if (known.length < lengths.length) return null;
  const mm = known.reduce((sum, { value }) => sum + value, 0);
  return {
    mm,
    how: `${formatLength(mm)} as the sum of the lengths of zones ${zone} to 5, ${pathWords(known)}, ${exam.imagingDate}`,
    used: known.map(({ key }) => key),
  };
}

const zoneOrder: readonly BeginZone[] = ["0", "1", "2", "3", "4", "5"];

const pathWords = (lengths: readonly { path: string }[]): string =>
  lengths.every(({ path }) => path === "centreline")
    ? "along the centreline"
    : "along a path that is not stated";

/** The descending thoracic aorta begins beyond the left subclavian artery, where zone 3 does. */
function ofDescending(patientCase: PatientCase, exam: Exam): AorticLength | null {
  const length = lengthAt(patientCase, exam, "descending-thoracic-aorta");
  return (
    length && {
      mm: length.value,
      how: `${formatLength(length.value)}, ${length.place.label}, ${pathWords([length])}, ${exam.imagingDate}`,
      used: [length.key],
    }
  );
}
