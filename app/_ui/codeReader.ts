/** Finds a code in what a video shows now; null where there is none. */
export type CodeReader = (video: HTMLVideoElement) => Promise<string | null>;

interface Detector {
  detect(source: HTMLVideoElement): Promise<readonly { rawValue: string }[]>;
}
interface DetectorKind {
  new (options: { formats: string[] }): Detector;
  getSupportedFormats(): Promise<string[]>;
}

/** The version that the code reader's address carries, so that it may be kept for good. */
const READER = "/api/zxing?v=3.1.2";

/** The browser's own reader where it has one for our codes, else zxing, fetched from our own server only now. */
export async function codeReader(): Promise<CodeReader> {
  const own = (globalThis as { BarcodeDetector?: DetectorKind }).BarcodeDetector;
  if (own) {
    const formats = await own.getSupportedFormats();
    if (formats.includes("code_128") && formats.includes("qr_code")) {
      const detector = new own({ formats: ["code_128", "qr_code"] });
      return async (video) => (await detector.detect(video))[0]?.rawValue ?? null;
    }
  }
  const { prepareZXingModule, readBarcodes } = await import("zxing-wasm/reader");
  await prepareZXingModule({ overrides: { locateFile: () => READER }, fireImmediately: true });
  const canvas = document.createElement("canvas");
  return async (video) => {
    const picture = pictureOf(video, canvas);
    if (!picture) return null;
    const [found] = await readBarcodes(picture, { formats: ["Code128", "QRCode"], maxNumberOfSymbols: 1 });
    return found?.isValid ? found.text : null;
  };
}

function pictureOf(video: HTMLVideoElement, canvas: HTMLCanvasElement): ImageData | null {
  const { videoWidth, videoHeight } = video;
  const pen = canvas.getContext("2d", { willReadFrequently: true });
  if (!pen || videoWidth === 0) return null;
  canvas.width = videoWidth;
  canvas.height = videoHeight;
  pen.drawImage(video, 0, 0);
  return pen.getImageData(0, 0, videoWidth, videoHeight);
}
