import js from '@eslint/js';
import globals from 'globals';

// Text from a file, a link or a field must never become markup, so every way
// to make markup of text is closed.
const markup = ['innerHTML', 'outerHTML', 'insertAdjacentHTML', 'setHTMLUnsafe', 'createContextualFragment', 'srcdoc'].map(
  (property) => ({ property, message: 'Text must not become markup: build elements with the helpers of app/dom.js.' }),
);

const rules = {
  'no-restricted-properties': [
    'error',
    ...markup,
    { object: 'document', property: 'write', message: 'Text must not become markup.' },
  ],
  'no-restricted-globals': ['error', { name: 'DOMParser', message: 'Text must not become markup.' }],
  'no-eval': 'error',
  'no-implied-eval': 'error',
  'no-new-func': 'error',
  'no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
  'prefer-const': 'error',
  'no-var': 'error',
  eqeqeq: 'error',
  'max-lines': ['error', { max: 450, skipBlankLines: false }],
};

export default [
  { ignores: ['node_modules/', '**/*.d.ts'] },
  js.configs.recommended,
  { files: ['app/**/*.js'], languageOptions: { globals: globals.browser }, rules },
  {
    files: ['worker/*.js', 'sw.js'],
    languageOptions: { sourceType: 'script', globals: { ...globals.worker, ...globals.serviceworker, Go: 'readonly' } },
    rules: { ...rules, 'no-unused-vars': ['error', { varsIgnorePattern: '^serveEngine$' }] },
  },
  {
    files: ['test/**/*.mjs', '*.config.js'],
    languageOptions: { globals: { ...globals.node, ...globals.browser } },
    rules: { 'prefer-const': 'error', 'no-var': 'error', eqeqeq: 'error' },
  },
];
