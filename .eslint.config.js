import tseslint from 'typescript-eslint'

export default tseslint.config(
  { ignores: ['node_modules/', '.data/', 'views/assets/'] },
  ...tseslint.configs.recommended,
  {
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off', // typed arrays are read by index that the loop bounds
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      'no-restricted-exports': ['error', { restrictDefaultExports: { direct: false } }],
    },
  },
)
