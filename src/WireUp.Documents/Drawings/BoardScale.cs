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

    /// <summary>
    /// The parts of the plan on each sheet, in rows from the top left as they are seen: the board, and a little of what lies beyond its far
    /// edges. The edges along which the rules stand are edges of the sheets too.
    /// </summary>
    public static ImmutableArray<PlanBox> Sheets(PlanBox board, SceneBox area, int scale, DrawingView view)
    {
        ImmutableArray<(double From, double To)> columns = Along(board.Width, area.Width, scale), rows = Along(board.Height, area.Height, scale);
        return
        [
            .. from row in rows.Reverse()
               from column in columns
               let left = view == DrawingView.Above ? board.MinX + column.From : board.MaxX - column.To
               select new PlanBox(left, board.MinY + row.From, left + column.To - column.From, board.MinY + row.To),
        ];
    }

    /// <summary>The window on paper for a part of the plan, in the middle of the area that there is.</summary>
    public static SceneBox WindowFor(PlanBox part, SceneBox area, int scale)
    {
        double width = part.Width * 1000 / scale, height = part.Height * 1000 / scale;
        return new(area.Centre.X - (width / 2), area.Centre.Y - (height / 2), area.Centre.X + (width / 2), area.Centre.Y + (height / 2));
    }

    /// <summary>Lengths of a board, in metres from the edge where its rule begins, each as long as a sheet shows.</summary>
    private static ImmutableArray<(double From, double To)> Along(double length, double millimetres, int scale)
    {
        const double OverlapMillimetres = 8, BeyondMillimetres = 12;
        double window = millimetres * scale / 1000, overlap = OverlapMillimetres * scale / 1000, all = length + (BeyondMillimetres * scale / 1000);
        int count = length <= window + 1e-9 ? 1 : (int)Math.Ceiling(((length - overlap) / (window - overlap)) - 1e-9);
        return [.. Enumerable.Range(0, count).Select(i => i * (window - overlap)).Select(from => (from, Math.Min(from + window, all)))];
    }
}
