import { readAcknowledgement } from './acknowledgement.ts';
import { readAddressClaim, industryGroupName } from './address-claim.ts';
import type { BusMessage } from './bus-message.ts';
import { abortReasonText, readControl, type ControlMessage } from './control-message.ts';
import { groupName, PGN } from './group-names.ts';
import { millis } from '../quantities/time.ts';
import { litLamps } from './lamp-words.ts';
import { readTroubleCodes } from './read-trouble-codes.ts';
import { sourceName } from './source-addresses.ts';
import { describeCode } from './trouble-code-words.ts';

/** One line beside a raw frame. `spn` is null for what is no parameter. */
export interface DecodedLine {
  readonly spn: number | null;
  readonly label: string;
  readonly text: string;
}

const line = (label: string, text: string): DecodedLine => ({ spn: null, label, text });

/** A group as number and name. */
const groupText = (pgn: number): string => (groupName(pgn) === null ? `${pgn}` : `${pgn}, ${groupName(pgn)}`);

/** What a message of the protocol itself says: requests, acknowledgements, transport, address claims, trouble codes. Empty for others. */
export function describeMessage(pgn: number, data: Uint8Array): DecodedLine[] {
  switch (pgn) {
    case PGN.request:
      return data.length < 3
        ? []
        : [line('asks for', groupText(data[0]! | (data[1]! << 8) | (data[2]! << 16)))];
    case PGN.transportControl:
      return controlLines(readControl(data));
    case PGN.transportData:
      return data.length === 0 ? [] : [line('packet', `${data[0]}`)];
    case PGN.acknowledgement:
      return acknowledgementLines(messageOf(pgn, data));
    case PGN.addressClaim:
      return claimLines(messageOf(pgn, data));
    case PGN.activeCodes:
    case PGN.previousCodes:
      return codeLines(data);
    default:
      return [];
  }
}

const messageOf = (pgn: number, data: Uint8Array): BusMessage => ({
  atMs: millis(NaN),
  pgn,
  origin: 0,
  destination: 0xff,
  data,
  carriage: 'single',
});

function controlLines(control: ControlMessage | null): DecodedLine[] {
  if (control === null) return [];
  const about = groupText(control.pgn);
  switch (control.kind) {
    case 'bam':
    case 'rts': {
      const how = control.kind === 'bam' ? 'announces to all (BAM)' : 'asks to send (RTS)';
      if (Number.isNaN(control.pgn)) return [line(how, 'too short')];
      return [line(how, `${about}: ${control.sizeBytes} bytes in ${control.packets} packets`)];
    }
    case 'cts':
      return control.packets === 0
        ? [line('asks to wait (CTS)', about)]
        : [line('asks for packets (CTS)', `${about}: ${control.packets} from ${control.next} on`)];
    case 'end':
      return [line('has all (end acknowledgement)', about)];
    case 'abort':
      return [line('aborts', `${about}: ${abortReasonText(control.reason)}`)];
  }
}

function acknowledgementLines(message: BusMessage): DecodedLine[] {
  const read = readAcknowledgement(message);
  if (!read) return [];
  const to = read.askedBy === null ? '' : ` to ${sourceName(read.askedBy) ?? read.askedBy}`;
  return [line(`${read.answer}${to}`, groupText(read.pgn))];
}

function claimLines(message: BusMessage): DecodedLine[] {
  const claim = readAddressClaim(message);
  if (!claim) return [];
  const group = industryGroupName(claim.industryGroup) ?? `${claim.industryGroup}`;
  return [
    line(
      'claims its address',
      `industry group ${group}, function ${claim.function}, identity number ${claim.identityNumber}`,
    ),
  ];
}

function codeLines(data: Uint8Array): DecodedLine[] {
  const report = readTroubleCodes(data, NaN);
  if (!report) return [];
  const lamps = litLamps(report.lamps);
  const codes = report.codes.map((code): DecodedLine => {
    const { what, how } = describeCode(code);
    return { spn: code.spn, label: what, text: `FMI ${code.fmi}: ${how}` };
  });
  return [
    line('lamps', lamps.length === 0 ? 'none lit' : lamps.join(', ')),
    ...(codes.length === 0 ? [line('trouble codes', 'none')] : codes),
  ];
}
