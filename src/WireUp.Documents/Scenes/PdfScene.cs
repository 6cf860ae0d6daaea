using SkiaSharp;

namespace WireUp.Documents;

/// <summary>Scenes as the pages of a PDF file, with searchable text and the font inside.</summary>
public static class PdfScene
{
    private const double PointsPerMillimetre = 72 / 25.4;

    /// <summary>One scene as a file of one page.</summary>
    public static byte[] Write(Scene scene) => Write([scene], new PdfProperties { Title = scene.Title });

    /// <summary>Each scene as one page of its own size. The same scenes and properties give the same bytes.</summary>
    /// <param name="pages">The pages; at least one.</param>
    /// <param name="properties">What the file says of itself.</param>
    public static byte[] Write(IReadOnlyCollection<Scene> pages, PdfProperties properties)
    {
        if (pages.Count == 0) throw new ArgumentException("a file needs at least one page", nameof(pages));
        using MemoryStream stream = new();
        using (SKDocument document = SKDocument.CreatePdf(stream, Metadata(properties)))
        {
            foreach (Scene page in pages)
            {
                SKCanvas canvas = document.BeginPage(Points(page.WidthMillimetres), Points(page.HeightMillimetres));
                canvas.Scale((float)PointsPerMillimetre);
                SkiaPainter.Paint(page, canvas);
                document.EndPage();
            }

            document.Close();
        }

        return stream.ToArray();
    }

    private static SKDocumentPdfMetadata Metadata(PdfProperties properties)
    {
        SKDocumentPdfMetadata metadata = SKDocumentPdfMetadata.Default;
        metadata.Title = SceneText.Clean(properties.Title);
        metadata.Creator = metadata.Producer = "WireUp";
        metadata.Creation = metadata.Modified = properties.Made;
        return metadata;
    }

    private static float Points(double millimetres) => (float)(millimetres * PointsPerMillimetre);
}

/// <summary>What a PDF file says of itself.</summary>
public sealed record PdfProperties
{
    /// <summary>The moment a file claims when nobody gives one: the start of the year 2000, plainly not a real one.</summary>
    public static readonly DateTime NoMoment = new(2000, 1, 1, 0, 0, 0, DateTimeKind.Utc);

    /// <summary>Title.</summary>
    public string Title { get; init; } = string.Empty;

    /// <summary>When it was made; given by the caller, never the clock.</summary>
    public DateTime Made { get; init; } = NoMoment;
}
