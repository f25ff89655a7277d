"""The bytes a device sends: the file of a form, or the whole body of anything else."""

from fastapi import HTTPException, Request
from starlette.datastructures import UploadFile


async def sent_file(request: Request, called: str) -> bytes:
    """Give them; raises `HTTPException` 422 for a form without one, `called` what it should have been."""
    if not request.headers.get("content-type", "").startswith("multipart/form-data"):
        return await request.body()
    async with request.form(max_files=1, max_fields=20) as form:
        file = form.get("file")
        if not isinstance(file, UploadFile):
            raise HTTPException(422, f"file: missing; expected {called} as `file`; choose it and send again")
        return await file.read()
