import svelte from 'eslint-plugin-svelte';
import { defineConfig } from 'eslint/config';
import ts from 'typescript-eslint';

const HTML_FROM_TEXT = 'Text never becomes HTML here: build elements, or let Svelte build them.';

export default defineConfig(
  { ignores: ['dist', 'coverage', 'node_modules', 'tests/pictures', 'tests/fixtures', '.cache'] },
  { files: ['**/*.ts', '**/*.svelte'], extends: [ts.configs.recommendedTypeChecked] },
  svelte.configs.recommended,
  {
    files: ['**/*.ts', '**/*.svelte'],
    languageOptions: {
      parserOptions: {
        projectService: true,
        tsconfigRootDir: import.meta.dirname,
        extraFileExtensions: ['.svelte'],
      },
    },
    rules: {
      eqeqeq: 'error',
      'no-undef': 'off', // the type checker knows better
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', varsIgnorePattern: '^_', ignoreRestSiblings: true },
      ],
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
    },
  },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { parserOptions: { parser: ts.parser } },
    rules: {
      'svelte/no-at-html-tags': 'error',
      'prefer-const': 'off', // props and state are declared with let
    },
  },
  {
    files: ['src/**'],
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'error',
      'no-console': 'error',
      'no-eval': 'error',
      'no-restricted-syntax': [
        'error',
        {
          selector:
            'MemberExpression[property.name=/^(innerHTML|outerHTML|insertAdjacentHTML|setHTMLUnsafe)$/]',
          message: HTML_FROM_TEXT,
        },
        {
          selector: "MemberExpression[object.name='document'][property.name=/^(write|writeln)$/]",
          message: HTML_FROM_TEXT,
        },
        {
          selector: "SvelteAttribute[key.name='innerHTML']",
          message: HTML_FROM_TEXT,
        },
        {
          selector: "SvelteAttribute[key.name='style']",
          message: 'The security policy refuses style attributes: use a class, or style:name={…}.',
        },
      ],
    },
  },
  { files: ['src/cli/**'], rules: { 'no-console': 'off' } },
  {
    files: ['tests/**'],
    rules: {
      // Fixtures and oracles are JSON written elsewhere; the checks themselves say what is in them.
      '@typescript-eslint/no-implied-eval': 'off', // the engine's own arithmetic is an oracle
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
      '@typescript-eslint/unbound-method': 'off',
    },
  },
);
