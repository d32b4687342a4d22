import tseslint from 'typescript-eslint'

export default tseslint.config(
  { ignores: ['node_modules/', '.data/', 'views/assets/'] },
  ...tseslint.configs.recommended,
  {
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off', // typed arrays are read by index that the loop bounds
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', ignoreRestSiblings: true }],
      'no-restricted-exports': ['error', { restrictDefaultExports: { direct: false } }],
    },
  },
  {
    // What only types can tell: a promise that nobody waits for fails where nobody sees it.
    files: ['**/*.ts'],
    languageOptions: { parserOptions: { projectService: true } },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': ['error', { checksVoidReturn: false }],
      '@typescript-eslint/await-thenable': 'error',
    },
  },
)
