import { SaxesParser } from 'saxes';

/** The texts that a strict XML parser finds; throws where the XML is not well-formed. */
export function textsInXml(svg: string): readonly string[] {
  const parser = new SaxesParser({ xmlns: true });
  const texts: string[] = [];
  let current: string | undefined;
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ local }) => {
    if (local === 'text' || local === 'title' || local === 'desc') current = '';
  });
  parser.on('text', (text) => {
    if (current !== undefined) current += text;
  });
  parser.on('closetag', ({ local }) => {
    if (current !== undefined && (local === 'text' || local === 'title' || local === 'desc')) {
      texts.push(current);
      current = undefined;
    }
  });
  parser.write(svg).close();
  return texts;
}
