using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Spectre.Console;
using Spectre.Console.Rendering;
using WireUp.Files;

namespace WireUp.Output;

/// <summary>The two streams: results on standard output, everything else (progress, complaints) on standard error.</summary>
internal sealed class Terminal
{
    /// <summary>Indented, with readable characters.</summary>
    public static readonly JsonSerializerOptions Pretty =
        new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private readonly TextReader _input = Console.In;
    private readonly TextWriter _results = Console.Out;
    private readonly TextWriter _remarks = Console.Error;
    private readonly bool _errorIsTerminal = !Console.IsErrorRedirected;
    private readonly IAnsiConsole _out = Create(Console.Out, Console.IsOutputRedirected);
    private readonly IAnsiConsole _error = Create(Console.Error, Console.IsErrorRedirected);

    /// <summary>Whether remarks are left out, and only results, problems and refusals printed.</summary>
    public bool IsQuiet { get; set; }

    /// <summary>Whether every step is told, a line each, also where nobody watches.</summary>
    public bool IsVerbose { get; set; }

    /// <summary>Whether a person watches standard error, so that progress is worth showing.</summary>
    public bool ShowsProgress => _errorIsTerminal && !IsQuiet && !IsVerbose;

    /// <summary>The console on standard error, for progress.</summary>
    public IAnsiConsole Error => _error;

    /// <summary>What is typed or piped into standard input, to its end.</summary>
    /// <exception cref="InputRefused">It is longer than that.</exception>
    public string ReadInput(long most)
    {
        char[] room = new char[81920];
        StringBuilder text = new();
        for (int read; (read = _input.Read(room, 0, room.Length)) > 0;)
        {
            if (text.Append(room, 0, read).Length > most)
            {
                throw new InputRefused("standard input is too long");
            }
        }

        return text.ToString();
    }

    /// <summary>Writes a result as it is.</summary>
    public void Write(string text) => _results.Write(text);

    /// <summary>Writes a result that may hold Spectre markup; names in it must be escaped.</summary>
    public void Markup(string markup) => _out.MarkupLine(markup);

    /// <summary>Writes a table, a rule, …</summary>
    public void Show(IRenderable renderable) => _out.Write(renderable);

    /// <summary>Writes one JSON document.</summary>
    public void Json(JsonNode node) => _results.WriteLine(node.ToJsonString(Pretty));

    /// <summary>Says what went wrong.</summary>
    public void Complain(string message) => _remarks.WriteLine($"wireup: {message}");

    /// <summary>Tells a problem of a file.</summary>
    public void Problem(string problem) => _remarks.WriteLine(problem);

    /// <summary>Says what was done, unless nothing of the kind is wanted.</summary>
    public void Note(string message)
    {
        if (!IsQuiet)
        {
            _remarks.WriteLine(message);
        }
    }

    private static IAnsiConsole Create(TextWriter writer, bool redirected)
    {
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(writer) });
        if (redirected)
        {
            // A pipe has no width of its own: wide enough that no table is broken over lines.
            console.Profile.Width = 160;
        }

        return console;
    }
}
