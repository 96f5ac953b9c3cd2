/** Words of the trade that the general dictionary lacks or says otherwise; phones as in the CMU dictionary. */
export const OWN_PRONUNCIATIONS: Readonly<Record<string, readonly string[]>> = {
  psi: ['P IY EH S AY'],
  gpm: ['JH IY P IY EH M'],
  kilopascals: ['K IH L OW P AE S K AH L Z', 'K IH L AH P AE S K AE L Z'],
  skimmer: ['S K IH M ER'],
  tester: ['T EH S T ER'],
  "cleaner's": ['K L IY N ER Z'],
  strainer: ['S T R EY N ER'],
  skimmers: ['S K IH M ER Z'],
  clogged: ['K L AA G D'],
  unclogged: ['AH N K L AA G D'],
  channelled: ['CH AE N AH L D'],
  slippery: ['S L IH P ER IY'],
  diatomaceous: ['D AY AH T AH M EY SH AH S'],
};
