import { InvalidArgumentError } from 'commander';
import {
  type SheetSizeName,
  sheetSizeNamed,
  sheetSizeNames,
} from '../../../language/domain/drawing/sheet/sheet-sizes.ts';

/** `--sheet 24x18`, in any letters. */
export function readSheetChoice(written: string): SheetSizeName {
  const size = sheetSizeNamed(written);
  if (size === undefined) throw new InvalidArgumentError(`There are ${sheetSizeNames.join(', ')}.`);
  return size;
}
