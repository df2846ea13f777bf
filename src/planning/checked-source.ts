/** Where a figure comes from, with how it was checked. */
export const checkedSource = ({
  source,
  confirmed,
}: {
  source: string;
  confirmed: boolean;
}): string => (confirmed ? source : `${source} (not confirmed against the source)`);
