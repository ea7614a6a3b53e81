import { useEffect, useRef, useState } from 'react';
import type { LabelAnswer, LabelPicture } from './label.worker.ts';

/** Reads a code from the camera or from a photograph. The reader is fetched only when this opens. */
export function CameraScan({ onText }: { readonly onText: (text: string) => void }) {
  const video = useRef<HTMLVideoElement>(null);
  const [said, setSaid] = useState('Hold the code of the label into the picture.');
  const [live, setLive] = useState(true);
  const found = useRef(onText);
  found.current = onText;
  const reader = useRef<LabelReader | null>(null);
  useEffect(() => {
    const eye = openReader();
    reader.current = eye;
    let stream: MediaStream | null = null;
    let wanted = true;
    const watch = async (): Promise<void> => {
      if (!navigator.mediaDevices) throw new Error('no camera');
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } });
      if (!wanted) return stopped(stream);
      const shown = video.current;
      if (!shown) return;
      shown.srcObject = stream;
      await shown.play();
      while (wanted) {
        const answer = await eye.look(frameOf(shown));
        if (!wanted) return;
        if (answer.ok && answer.text) return found.current(answer.text);
        if (!answer.ok) return setSaid(`The picture could not be read: ${answer.message}`);
        await new Promise((done) => setTimeout(done, 120));
      }
    };
    watch().catch(() => {
      setLive(false);
      setSaid('No camera can be used here. Choose a photograph of the label, or paste its text above.');
    });
    return () => {
      wanted = false;
      if (stream) stopped(stream);
      eye.close();
    };
  }, []);
  const photograph = async (file: File | undefined): Promise<void> => {
    if (!file || !reader.current) return;
    const answer = await reader.current.look(file);
    if (answer.ok && answer.text) onText(answer.text);
    else setSaid(answer.ok ? 'No code was found in this picture.' : `The picture could not be read: ${answer.message}`);
  };
  return (
    <div className="camera">
      {live && <video ref={video} muted playsInline aria-label="Picture of the camera" />}
      <p role="status">{said}</p>
      <label className="button">
        Photograph of a label
        <input
          className="unseen"
          type="file"
          accept="image/*"
          onChange={(event) => void photograph(event.target.files?.[0])}
        />
      </label>
    </div>
  );
}

const stopped = (stream: MediaStream): void => {
  for (const track of stream.getTracks()) track.stop();
};

function frameOf(video: HTMLVideoElement): ImageData {
  const canvas = new OffscreenCanvas(video.videoWidth, video.videoHeight);
  const context = canvas.getContext('2d');
  if (!context) throw new Error('this browser has no canvas');
  context.drawImage(video, 0, 0);
  return context.getImageData(0, 0, canvas.width, canvas.height);
}

interface LabelReader {
  readonly look: (picture: ImageData | Blob) => Promise<LabelAnswer>;
  readonly close: () => void;
}

/** A reader in a thread of its own; its files come from this server. */
function openReader(): LabelReader {
  const worker = new Worker(new URL('label.worker.js', document.baseURI), { type: 'module' });
  const wasm = new URL('zxing_reader.wasm', document.baseURI).href;
  return {
    look: (picture) =>
      new Promise((done) => {
        worker.addEventListener('message', (event: MessageEvent<LabelAnswer>) => done(event.data), { once: true });
        worker.addEventListener('error', () => done({ ok: false, message: 'the reader did not start' }), {
          once: true,
        });
        worker.postMessage({ picture, wasm } satisfies LabelPicture);
      }),
    close: () => worker.terminate(),
  };
}
