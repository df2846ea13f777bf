/** What the checks use of packages that bring no types. */
declare module "csv-spectrum" {
  type Sample = { name: string; csv: Uint8Array; json: Uint8Array };
  export default function spectrum(done: (error: Error | null, samples: Sample[]) => void): void;
}

declare module "@lhncbc/ucum-lhc" {
  interface Conversion {
    status: "succeeded" | "failed" | "error";
    toVal: number | null;
  }
  const ucum: {
    UcumLhcUtils: {
      getInstance(): {
        convertUnitTo(from: string, value: number, to: string): Conversion;
        validateUnitString(unit: string): { status: "valid" | "invalid" | "error" };
      };
    };
  };
  export default ucum;
}
