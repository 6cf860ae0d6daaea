namespace WireUp.Documents.Tests.Scenes;

/// <summary>Small scenes for the tests of the writers.</summary>
internal static class SceneSamples
{
    /// <summary>Names that break a careless writer: markup, quotes, control characters, reversed reading.</summary>
    public static readonly TheoryData<string> HostileNames =
    [
        "<script>alert(1)</script>", "\"quoted\" & 'so'", "]]>", "-->", "tab\tbell\u0007nul\0", "\u202Egnp.exe", "‏שלום‏", "عربي",
        "lone \uD800 half", "\uFFFE", "&amp;", "naïve Ω °C ≤ ½", "=1+1",
    ];

    /// <summary>One shape of each kind, all named after the argument.</summary>
    public static Scene Named(string name) => new(60, 40,
    [
        new Shape.Line("rails", [new(5, 5), new(55, 5), new(50, 20)], true, new() { Stroke = SceneColours.Blue, Dash = DashKind.Long }) { Id = name },
        new Shape.Circle("names", new(30, 25), 4, ShapeStyle.Area(SceneColours.Orange)) { Id = name },
        new Shape.Text("names", new(30, 35), name, new(4, SceneColours.Ink) { Align = TextAlign.Middle }) { Id = name },
    ])
    {
        Title = name,
    };
}
