using System.Diagnostics;
using System.Text.Json.Nodes;

namespace WireUp.Acceptance.Tests.Program;

/// <summary>Runs the built program as a person does: a process of its own, in a folder of its own.</summary>
internal static class Wireup
{
    public static Task<Outcome> RunAsync(string folder, params string[] arguments) => RunAsync(folder, null, arguments);

    /// <summary>Runs it with something piped in.</summary>
    public static async Task<Outcome> RunAsync(string folder, string? input, string[] arguments, params (string Name, string Value)[] environment)
    {
        ProcessStartInfo start = new("dotnet")
        {
            WorkingDirectory = folder,
            UseShellExecute = false,
            RedirectStandardInput = input is not null,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "wireup.dll"));
        foreach (string argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        foreach ((string name, string value) in environment)
        {
            start.Environment[name] = value;
        }

        using Process process = Process.Start(start)!;
        if (input is not null)
        {
            await process.StandardInput.WriteAsync(input);
            process.StandardInput.Close();
        }

        Task<string> output = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        Task<string> error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return new(process.ExitCode, await output, await error);
    }

    internal sealed record Outcome(int ExitCode, string Output, string Error)
    {
        public JsonObject Json => JsonNode.Parse(Output)!.AsObject();

        public override string ToString() => $"exit {ExitCode}\n--- out\n{Output}\n--- error\n{Error}";
    }
}
