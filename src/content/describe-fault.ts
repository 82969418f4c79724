import type { ErrorCode } from 'yaml'

/** What is wrong with a YAML text, by the parser's code: its own message quotes the text, which may be about a person. */
export const describeFault: Record<ErrorCode, string> = {
  ALIAS_PROPS: 'has an alias with properties',
  BAD_ALIAS: 'has an alias that cannot be read',
  BAD_COLLECTION_TYPE: 'has a tag that does not fit',
  BAD_DIRECTIVE: 'has a directive that is not known',
  BAD_DQ_ESCAPE: 'has a backslash that means nothing between double quotes',
  BAD_INDENT: 'is indented wrongly, or has a bracket that is not closed',
  BAD_PROP_ORDER: 'has a tag or an anchor in the wrong place',
  BAD_SCALAR_START: 'has a text that begins with a reserved sign and is not in quotes',
  BLOCK_AS_IMPLICIT_KEY: 'has a colon too many, or a text with a colon that is not in quotes',
  BLOCK_IN_FLOW: 'has an indented block between brackets',
  DUPLICATE_KEY: 'has a key twice in one place',
  IMPOSSIBLE: 'cannot be read',
  KEY_OVER_1024_CHARS: 'has a key that is too long',
  MISSING_CHAR: 'lacks a sign: a quote, a colon, a comma or a bracket',
  MULTILINE_IMPLICIT_KEY: 'has a key that runs over several lines, or lacks a colon',
  MULTIPLE_ANCHORS: 'has two anchors in one place',
  MULTIPLE_DOCS: 'holds more than one document',
  MULTIPLE_TAGS: 'has two tags in one place',
  NON_STRING_KEY: 'has a key that is no text',
  RESOURCE_EXHAUSTION: 'is nested too deeply',
  TAB_AS_INDENT: 'is indented with a tab',
  TAG_RESOLVE_FAILED: 'has a tag that is not known',
  UNEXPECTED_TOKEN: 'has something here that does not belong',
}
