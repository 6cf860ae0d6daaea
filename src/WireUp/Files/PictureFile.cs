using WireUp.Documents;

namespace WireUp.Files;

/// <summary>Writes a sheet as the kind of picture that a file's name asks for.</summary>
internal static class PictureFile
{
    /// <summary>Refuses a name that does not end as a picture's does, before any work is done for it.</summary>
    /// <exception cref="InputRefused">It ends in something else.</exception>
    public static void Check(FileInfo file)
    {
        if (file.Extension.ToUpperInvariant() is not (".SVG" or ".PNG" or ".PDF"))
        {
            throw new InputRefused($"'{file.Name}' should end in .svg, .png or .pdf");
        }
    }

    /// <summary>Writes the picture.</summary>
    /// <exception cref="InputRefused">The name ends in something else, or the file cannot be written.</exception>
    public static void Write(FileInfo file, Scene scene)
    {
        Check(file);
        switch (file.Extension.ToUpperInvariant())
        {
            case ".SVG":
                LayoutFiles.Write(file, SvgScene.Write(scene));
                break;
            case ".PNG":
                LayoutFiles.Write(file, PngScene.Write(scene));
                break;
            default:
                LayoutFiles.Write(file, PdfScene.Write(scene));
                break;
        }
    }
}
