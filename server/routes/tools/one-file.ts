import type { RequestHandler } from 'express'
import multer, { MulterError } from 'multer'
import { BadRequest } from '../../errors.js'

/** A form that brings one file along, in memory as `req.file`; its other fields are in `req.body`. */
export function oneFile(field: string, mostBytes: number): RequestHandler {
  const parse = multer({
    limits: { fileSize: mostBytes, files: 1, fieldSize: mostBytes, fields: 8 },
  }).single(field) as RequestHandler
  return (req, res, next) => {
    void parse(req, res, (error?: unknown) => {
      if (!(error instanceof MulterError)) return next(error)
      const tooLong = error.code === 'LIMIT_FILE_SIZE' || error.code === 'LIMIT_FIELD_VALUE'
      next(
        new BadRequest(
          tooLong
            ? `The file is larger than ${Math.floor(mostBytes / 1000)} kB; choose a smaller one.`
            : 'That did not come from a form of this page. Open the page again and send it from there.',
          { field, status: tooLong ? 413 : 400 },
        ),
      )
    })
  }
}
