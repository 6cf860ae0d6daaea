using System.Collections.Immutable;
using QRCoder;

namespace WireUp.Documents.Book;

/// <summary>Draws a QR code (ISO/IEC 18004) of a text. The encoder is a library's; the squares are drawn as strokes, row by row.</summary>
internal static class QrCode
{
    /// <summary>Smallest side of one square that a usual camera and printer manage, in millimetres. Common practice, no published source.</summary>
    public const double LeastModule = 0.33;

    /// <summary>The code as large as a side allows, with its quiet margin; null where its squares would be too small to be read.</summary>
    /// <param name="text">What it says.</param>
    /// <param name="corner">Its upper left corner.</param>
    /// <param name="side">Side of the square it may fill, margin included, in millimetres.</param>
    public static Shape? Draw(string text, ScenePoint corner, double side)
    {
        using QRCodeData data = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.M, forceUtf8: true);
        int size = data.ModuleMatrix.Count;
        double module = side / size;
        if (module < LeastModule) return null;
        ImmutableArray<ScenePoint>.Builder strokes = ImmutableArray.CreateBuilder<ScenePoint>();
        for (int row = 0; row < size; row++)
        {
            for (int column = 0; column < size; column++)
            {
                if (!data.ModuleMatrix[row][column]) continue;
                int from = column;
                while (column < size && data.ModuleMatrix[row][column]) column++;
                double y = corner.Y + ((row + 0.5) * module);
                strokes.AddRange(new ScenePoint(corner.X + (from * module), y), new ScenePoint(corner.X + (column * module), y));
            }
        }

        return new Shape.Strokes("codes", strokes.ToImmutable(), ShapeStyle.Outline(SceneColours.Ink, module * 1.01)) { Id = text };
    }
}
