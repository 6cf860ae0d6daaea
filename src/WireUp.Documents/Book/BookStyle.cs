namespace WireUp.Documents.Book;

/// <summary>Sizes of the book in millimetres: one place decides how its pages look.</summary>
internal static class BookStyle
{
    /// <summary>Paper left free at the sides.</summary>
    public const double Side = 18;

    /// <summary>Paper left free above, with the running head in it.</summary>
    public const double Top = 22;

    /// <summary>Paper left free below, with the page number in it.</summary>
    public const double Bottom = 18;

    /// <summary>Height of a line as a part of the size of its font.</summary>
    public const double Leading = 1.42;

    public static readonly TextStyle Title = new(9.5, SceneColours.Ink) { Bold = true };
    public static readonly TextStyle Heading = new(5.4, SceneColours.Ink) { Bold = true };
    public static readonly TextStyle Subheading = new(3.5, SceneColours.Ink) { Bold = true };
    public static readonly TextStyle Body = new(3, SceneColours.Ink);
    public static readonly TextStyle Strong = Body with { Bold = true };
    public static readonly TextStyle Small = new(2.45, SceneColours.Quiet);
    public static readonly TextStyle Cell = new(2.65, SceneColours.Ink);
    public static readonly TextStyle CellStrong = Cell with { Bold = true };
    public static readonly TextStyle CellHead = new(2.4, SceneColours.Quiet) { Bold = true };

    /// <summary>Hair lines.</summary>
    public static readonly ShapeStyle Rule = ShapeStyle.Outline(SceneColours.Hair, 0.2);

    /// <summary>A line under the head of a table.</summary>
    public static readonly ShapeStyle HeadRule = ShapeStyle.Outline(SceneColours.Ink, 0.25);
}
