using System.Collections.Immutable;
using System.CommandLine;
using UnitsNet;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Layouts.Tracing;
using WireUp.Layouts.Tracing.Svg;
using WireUp.Output;

namespace WireUp.Commands;

/// <summary><c>wireup import</c>: a layout of the centre lines of an SVG drawing.</summary>
internal sealed class ImportVerb(Terminal terminal)
{
    private static readonly Argument<FileInfo> Drawing = new("drawing") { Description = "The drawing, *.svg." };
    private static readonly Option<FileInfo> Out = new("--out", "-o") { Description = "The layout file to write.", Required = true };
    private static readonly Option<string> Scale = new("--scale") { Description = "The railway's scale: Z, N, TT, HO, OO, S, O, 1, G.", DefaultValueFactory = _ => "HO" };
    private static readonly Option<string> Name = new("--name") { Description = "The railway's name; that of the drawing unless said." };
    private static readonly Option<string> Width = new("--width") { Description = "How wide the page of the drawing is in reality: '3.2 m'." };
    private static readonly Option<string> Unit = new("--unit") { Description = "How long one unit of the drawing is in reality: '1 = 1 mm'." };
    private static readonly Option<string> Layer = new("--layer") { Description = "Take only the lines of this layer or named group." };
    private static readonly Option<string> Stroke = new("--stroke") { Description = "Take only lines of this colour: '#c00000'." };
    private static readonly Option<string> Snap = new("--snap") { Description = "Ends this near to each other, or to a line, meet.", DefaultValueFactory = _ => "10 mm" };
    private static readonly Option<string> Longest = new("--longest-train") { Description = "Your longest train; reversing sections are sized by it.", DefaultValueFactory = _ => "1.2 m" };
    private static readonly Option<string[]> Answer = new("--answer") { Description = "An answer to a question of an earlier import: crossing-1=bridge. May be repeated." };
    private static readonly Option<bool> Replace = new("--replace") { Description = "Write over the layout file where there is one." };
    private static readonly Option<bool> Json = Common.Json();

    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        VerbCommand command = new("import", """
            Makes a layout of the lines of an SVG drawing.

            Draw the centre line of every track, in any drawing program, and save it as SVG. Lines whose ends touch go on
            into each other. A line that ends on another leaves it by a turnout; which way, and its frog number, is read off
            the directions. Where two lines cross, a crossing is taken; where that is not sure it says so, and takes another
            answer with --answer. Put everything that is not track on a layer of its own, or give it another colour.

            The size must be known: give --width, or --unit, or save the drawing full size in mm, cm or inches.

            Examples:
              wireup import attic.svg -o attic.layout.yaml --width '3.2 m'
              wireup import attic.svg -o attic.layout.yaml --unit '1 = 1 mm' --scale N --layer track
              wireup import attic.svg -o attic.layout.yaml --width '3.2 m' --stroke '#c00000' --answer crossing-1=bridge --replace
              wireup check attic.layout.yaml

            Ends with 0 when the layout was written, 2 when the drawing cannot be read. More: docs/import.md
            """)
        {
            Drawing, Out, Scale, Name, Width, Unit, Layer, Stroke, Snap, Longest, Answer, Replace, Json,
        };
        command.Runs<ImportVerb>((verb, parsed, _) => Task.FromResult(verb.Run(parsed)));
        return command;
    }

    private int Run(ParseResult parsed)
    {
        FileInfo drawing = parsed.GetRequiredValue(Drawing), target = parsed.GetRequiredValue(Out);
        if (target.Exists && !parsed.GetValue(Replace))
        {
            throw new InputRefused($"'{target}' exists already and is left as it is; choose another name, or add --replace");
        }

        SvgReading read = Read(LayoutFiles.DrawingText(drawing), parsed);
        TracedLayout traced = Trace(read, drawing, parsed);
        string text = TracedText.Write(traced, $"{drawing.Name}, 1 unit = {LengthWords(read.UnitMetres)}");
        LayoutReading back = LayoutFile.Read(text, target.Name);
        if (back.Layout is null)
        {
            throw new InputRefused($"the lines do not make a layout: {back.Problems[0].Message}");
        }

        LayoutFiles.Write(target, text);
        if (parsed.GetValue(Json))
        {
            terminal.Json(ImportText.Json(read, traced, target.ToString()));
        }
        else
        {
            ImportText.Write(terminal, read, traced);
            terminal.Note($"wrote {target}; next: wireup check {target}");
        }

        return ExitCode.Fine;
    }

    private static SvgReading Read(string text, ParseResult parsed)
    {
        if (parsed.GetValue(Width) is not null && parsed.GetValue(Unit) is not null)
        {
            throw new InputRefused("--width and --unit both say how large the drawing is; give one of them");
        }

        (SvgReading? reading, string? trouble) = SvgDrawing.Read(text, new()
        {
            Layer = parsed.GetValue(Layer),
            Stroke = parsed.GetValue(Stroke),
            Width = parsed.GetValue(Width) is { } width ? LengthOf("--width", width) : null,
            Unit = parsed.GetValue(Unit) is { } unit ? UnitOf(unit) : null,
        });
        return reading ?? throw new InputRefused($"'{parsed.GetRequiredValue(Drawing).Name}' cannot be traced: {trouble}");
    }

    private static TracedLayout Trace(SvgReading read, FileInfo drawing, ParseResult parsed)
    {
        string scale = parsed.GetRequiredValue(Scale);
        if (ScaleTable.Find(scale) is null)
        {
            throw new InputRefused($"--scale '{scale}' is no scale; expected {string.Join(", ", ScaleTable.All.Select(row => row.Name))}");
        }

        (TracedLayout? traced, string? trouble) = LineTracer.Trace(read.Lines, new()
        {
            Name = parsed.GetValue(Name) ?? Path.GetFileNameWithoutExtension(drawing.Name),
            Scale = scale,
            LongestTrain = LengthOf("--longest-train", parsed.GetRequiredValue(Longest)),
            SnapMetres = LengthOf("--snap", parsed.GetRequiredValue(Snap)).Meters,
            Answers = AnswersOf(parsed.GetValue(Answer) ?? []),
        });
        return traced ?? throw new InputRefused($"'{drawing.Name}' cannot be traced: {trouble}");
    }

    private static Length LengthOf(string option, string typed) => Common.Value(LayoutWords.Length(typed), $"{option} '{typed}'");

    /// <summary><c>1 = 1 mm</c>, <c>10 = 1 in</c>, or the length of one unit alone.</summary>
    private static Length UnitOf(string typed)
    {
        string[] parts = typed.Split('=', 2);
        Length length = Common.Value(LayoutWords.Length(parts[^1].Trim()), $"--unit '{typed}'");
        double units = parts.Length == 1 ? 1
            : double.TryParse(parts[0], System.Globalization.CultureInfo.InvariantCulture, out double number) && number is > 1e-6 and < 1e9 ? number
            : throw new InputRefused($"--unit '{typed}': expected units of the drawing, an equals sign and a length, such as '1 = 1 mm'");
        return length / units;
    }

    private static ImmutableDictionary<string, string> AnswersOf(string[] typed)
    {
        Dictionary<string, string> answers = new(StringComparer.Ordinal);
        foreach (string answer in typed)
        {
            string[] parts = answer.Split('=', 2);
            answers[parts[0].Trim()] = parts.Length == 2 ? parts[1].Trim() : throw new InputRefused($"--answer '{answer}': expected a question and an answer, such as crossing-1=bridge");
        }

        return answers.ToImmutableDictionary();
    }

    private static string LengthWords(double metres) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{metres * 1000:0.####} mm");
}
