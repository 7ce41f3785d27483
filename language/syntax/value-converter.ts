import { type CstNode, DefaultValueConverter, type GrammarAST, type ValueType } from 'langium';

/** Token text to the value in the tree. Lengths and quantities stay as typed: lowering reads them. */
export class SheetValueConverter extends DefaultValueConverter {
  protected override runConverter(rule: GrammarAST.AbstractRule, input: string, cstNode: CstNode): ValueType {
    switch (rule.name) {
      case 'ID':
        // A keyword used as a name prints as declared.
        return cstNode.text;
      case 'STRING':
      case 'OPEN_STRING':
        return unquote(input);
      case 'Count':
      case 'Penny':
        return readNumber(input);
      default:
        return input;
    }
  }
}

/** `\"` and `\\` stand for themselves; a string that lost its last quote keeps its text. */
function unquote(text: string): string {
  if (text.startsWith('“')) return text.slice(1, text.endsWith('”') ? -1 : undefined);
  const closed = /^"(?:\\.|[^"\\])*"$/.test(text);
  return text.slice(1, closed ? -1 : undefined).replace(/\\(.)/g, '$1');
}

/** `12`, `-3` (with either minus), `8d`. */
function readNumber(text: string): number {
  return Number.parseFloat(text.replace('−', '-'));
}
