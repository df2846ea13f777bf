/** The parts of dcmjs 0.52.2 that this project uses; the package ships no types. */
declare module "dcmjs" {
  /** A data set as dcmjs holds it: eight hexadecimal digits to value representation and values. */
  export interface DcmjsDataSet {
    [tag: string]: { vr: string; Value?: unknown[]; _rawValue?: unknown };
  }

  interface DcmjsFile {
    meta: DcmjsDataSet;
    dict: DcmjsDataSet;
    write(): ArrayBuffer;
  }

  const dcmjs: {
    log: { setLevel(level: "silent"): void };
    data: {
      DicomDict: new (meta: DcmjsDataSet) => DcmjsFile;
      DicomMessage: { readFile(file: ArrayBuffer): DcmjsFile };
      DicomMetaDictionary: { dictionary: Record<string, { vr: string } | undefined> };
    };
  };
  export default dcmjs;
}
