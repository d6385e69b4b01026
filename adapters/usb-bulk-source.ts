/** Reads under way at once, so that the bridge is heard while the page is busy; an operating system's driver does the same. */
const IN_FLIGHT = 4;
/** Bytes asked for by one read: a multiple of every bulk packet size there is (64 or 512). A short packet ends it early. */
const TRANSFER_BYTES = 16_384;
/** Bytes kept for a busy page before no more is asked for. */
const KEPT_BYTES = 65_536;

/** The members of a USBDevice that reading needs. */
export interface BulkDevice {
  transferIn(endpointNumber: number, length: number): Promise<USBInTransferResult>;
  clearHalt(direction: USBDirection, endpointNumber: number): Promise<void>;
}

/**
 * The bytes of one bulk endpoint as a stream. It errors with a DOMException named as Web Serial names it; `onBroken` is called
 * just before, so that the port gives a new stream next. A stall is cleared first, else the next read would stall too.
 *
 * Why not the polyfill's own stream: its `pull` does not wait for the read it starts, so each chunk leaves one more read
 * under way for ever (200 chunks: 201 reads; tests/adapters/web-usb.test.ts). Here never more than IN_FLIGHT are.
 */
export function usbBulkSource(
  device: BulkDevice,
  endpointNumber: number,
  onBroken: () => void,
): ReadableStream<Uint8Array> {
  const waiting: Promise<USBInTransferResult>[] = [];
  let cancelled = false;
  const nextResult = (): Promise<USBInTransferResult> => {
    while (waiting.length < IN_FLIGHT) {
      const read = device.transferIn(endpointNumber, TRANSFER_BYTES);
      read.catch(() => undefined); // reads that were never waited for end with the device
      waiting.push(read);
    }
    return waiting.shift()!;
  };
  /** Reads until there is something: a `pull` that enqueues nothing is not called again. */
  const readSome = async (): Promise<Uint8Array> => {
    for (;;) {
      const { status, data } = await nextResult();
      if (status === 'stall') {
        await device.clearHalt('in', endpointNumber);
        throw new DOMException('the USB endpoint stalled', 'UnknownError');
      }
      if (status === 'babble') throw new DOMException('more came than was asked for', 'BufferOverrunError');
      if (cancelled) return new Uint8Array();
      if (data && data.byteLength > 0) return new Uint8Array(data.buffer, data.byteOffset, data.byteLength);
    }
  };
  const pull = async (controller: ReadableStreamDefaultController<Uint8Array>) => {
    try {
      const bytes = await readSome();
      if (!cancelled) controller.enqueue(bytes);
    } catch (error) {
      if (cancelled) return;
      onBroken();
      controller.error(error);
    }
  };
  const cancel = () => void (cancelled = true);
  return new ReadableStream({ pull, cancel }, new ByteLengthQueuingStrategy({ highWaterMark: KEPT_BYTES }));
}
