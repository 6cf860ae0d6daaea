using System.Collections.Immutable;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>Scales of drawings of boards, and the sheets that a board takes at one.</summary>
internal static class BoardScale
{
    /// <summary>One millimetre on paper for so many on the railway. Source: ISO 5455.</summary>
    private static readonly ImmutableArray<int> Metric = [1, 2, 5, 10, 20, 50, 100];

    /// <summary>The scales of an architect's rule, from full size to a sixteenth of an inch to the foot. Common practice, no published source.</summary>
    private static readonly ImmutableArray<int> Feet = [1, 2, 4, 8, 12, 16, 24, 32, 48, 64, 96, 128, 192];

    /// <summary>The largest usual scale at which every board fits a window; the smallest where none does.</summary>
    public static int Fitting(ImmutableArray<PlanOutline> boards, SceneBox window, LengthStyle lengths)
    {
        PlanBox[] boxes = [.. boards.Select(board => PlanBox.Around(board.Corners))];
        ImmutableArray<int> usual = lengths == LengthStyle.Feet ? Feet : Metric;
        return usual.FirstOrDefault(scale => boxes.All(box => box.Width * 1000 / scale <= window.Width && box.Height * 1000 / scale <= window.Height), usual[^1]);
    }

    /// <summary>The parts of the plan on each sheet, each as large as a window at that scale: one in the middle of which the board lies, or rows of them from the top left.</summary>
    public static ImmutableArray<PlanBox> Sheets(PlanBox board, SceneBox window, int scale)
    {
        const double Overlap = 8;
        double width = window.Width * scale / 1000, height = window.Height * scale / 1000, overlap = Overlap * scale / 1000;
        (int columns, double left) = Along(board.MinX, board.Width, width, overlap);
        (int rows, double bottom) = Along(board.MinY, board.Height, height, overlap);
        return
        [
            .. from row in Enumerable.Range(0, rows)
               from column in Enumerable.Range(0, columns)
               let x = left + (column * (width - overlap))
               let y = bottom + ((rows - 1 - row) * (height - overlap))
               select new PlanBox(x, y, x + width, y + height),
        ];
    }

    /// <summary>How many windows cover a length, and where the first begins, so that what is over lies equally on both sides.</summary>
    private static (int Count, double First) Along(double from, double length, double window, double overlap)
    {
        int count = length <= window + 1e-9 ? 1 : (int)Math.Ceiling(((length - overlap) / (window - overlap)) - 1e-9);
        double covered = (count * (window - overlap)) + overlap;
        return (count, from - ((covered - length) / 2));
    }
}
